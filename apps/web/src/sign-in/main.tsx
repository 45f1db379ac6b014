import '../styles/base.css';
import '../styles/parts.css';
import './sign-in.css';
import './tablet.css';
import { createRoot } from 'react-dom/client';
import { SignInPage } from './sign-in-page.js';

const root = document.getElementById('root');
if (root) createRoot(root).render(<SignInPage />);
